"""What every page stands in: the shell, signing in, who asks, what is told where something is wrong."""
