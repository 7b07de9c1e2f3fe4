"""Where the app runs: one adapter a host, one set of ports (`ports.py`) that the screens see."""
