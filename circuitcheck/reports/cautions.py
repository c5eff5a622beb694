"""What every report says of itself."""

CAUTION = (
    "This does not replace local electrical codes, a risk assessment or a qualified person. Moving machinery "
    "can crush: test with the mechanism guarded and the supply current-limited."
)

MOTION_CAUTION = (
    "Reckoned from the figures in the plan, not measured. Motors, gears and props differ: try the stop slowly, with "
    "somebody at the emergency stop, before you rely on it."
)

NOT_LOOKED_AT = (
    "welded contacts and most broken wires, arcs, the size of wires (`size` looks at it), how far a motor runs on "
    "whose figures the plan doesn't give"
)
"""What no check asks yet; said where nothing was found, since nobody else would think of it."""
