"""The trade of the office room: money of the shop: amounts, invoices, numbers, guarantee."""
