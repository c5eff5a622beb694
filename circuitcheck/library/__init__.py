"""Many plans: what is asked of each, which are examined anew, and what is known of all of them together."""
