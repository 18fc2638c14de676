"""Tables of the people: customers and staff."""
