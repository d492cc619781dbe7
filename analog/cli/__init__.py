"""The command line: parse, call one library function, render, translate errors. It knows nothing of its own."""
