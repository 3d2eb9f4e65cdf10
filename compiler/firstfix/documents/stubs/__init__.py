"""Per-device settings: a sheet for whoever keys them in by hand, and the same as RFC 7951 instance data."""
