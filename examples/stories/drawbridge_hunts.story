# Shows: told to raise from the middle, the deck without steering diodes goes down instead, and then to and fro for ever.
# Plan: wrong/drawbridge_feeds_back.plan

begin S1 raise, deck between bottom and top, PS off
PS on
START pressed
START released
run
