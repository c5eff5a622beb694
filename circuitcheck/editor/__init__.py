"""Plans while they are being written: what an editor asks, answered from drafts that may be half finished."""
