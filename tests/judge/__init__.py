"""The judge: what holds in ONE state, worked out in the plainest way, to compare the sets of states with.

It knows a circuit's types and nothing of analysis/ or checks/. Where it and they differ, one of them is wrong.
"""
