"""What building the site is made of: packages, snapshot, client, worker, and the cache list."""
