"""Writing what is no entry: small functions, one commit each."""
