"""Tables of the counter: units, jobs, what was said and agreed, handing back."""
