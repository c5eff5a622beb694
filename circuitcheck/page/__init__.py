"""What the live page holds: the engine's own sets of states, so that the page only looks things up."""
