"""Changes of a plan's text that put a finding right, each tried before it is offered."""
