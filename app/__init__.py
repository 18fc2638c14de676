"""Spindlebook: the shop's book for a workshop that mends optical-disc players."""

__version__ = "0.1.0"
