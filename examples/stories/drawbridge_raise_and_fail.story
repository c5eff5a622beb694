# Shows: the deck goes up, stops at its limit, and a power failure on the way down leaves it braked until START.
# Plan: right/drawbridge.plan
#
# S1 begins at lower with the deck down, as after the last show. K2 is operated then, and when S1 is turned to raise it
# lets go a moment after K1 pulls in: see M1 in step 7. `K2 first` before the second turn shows the other order.

begin PS on, ES1 released, S1 lower, deck at bottom

START pressed
START released
S1 raise
deck to top

K2 first
S1 lower
run deck 1 zone
PS off
PS on
run
START pressed
START released
deck to bottom
