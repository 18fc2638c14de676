"""The counter: players taken in, the list of jobs, what was said and agreed, handing back."""
