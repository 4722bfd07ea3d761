"""The sections of a report on a session, one a module; `session_document` puts them in order."""
