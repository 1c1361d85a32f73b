"""Who may come in, and what the browser may do with what it gets: small middlewares, one idea each."""
