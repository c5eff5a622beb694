"""Whether wires, fuses, contacts and the rest can take the currents that flow: tables, arithmetic, verdicts."""
