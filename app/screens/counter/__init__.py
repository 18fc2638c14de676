"""The Counter place: jobs in the shop, taking in, handing back, customers, what was said."""
