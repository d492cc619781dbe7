"""`python -m analog` is the command `analog`."""

from analog.cli.main import run

if __name__ == "__main__":
    run()
