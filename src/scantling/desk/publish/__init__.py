"""Print and publish: the packet made beside the work, opened and downloaded."""
