"""The kinds of remarks, one a file: each yields what stands out in a session, and says why it matters."""
