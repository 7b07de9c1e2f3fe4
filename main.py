"""Where a native package begins: `flet build` looks for this file (see [tool.flet] in pyproject.toml)."""

from fieldapp.hosts.packaged import main

if __name__ == "__main__":
    main()
