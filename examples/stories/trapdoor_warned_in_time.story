# Shows: DROP let go before the three seconds are over drops nothing; held on, the timer pulls the latch.
# Plan: right/trapdoor_lantern.plan

S1 armed
press DROP
release DROP

press DROP
wait
release DROP
S1 off
