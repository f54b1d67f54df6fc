"""The mule file: read, written, migrated, its parts resolved, its names turned into linked things."""
