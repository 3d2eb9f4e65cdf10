"""What has been done so far on a real site: read from a small file beside the plan, written there, laid over the plan."""
