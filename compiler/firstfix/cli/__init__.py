"""The command line: arguments, printing, exit codes; no thinking. A module a command, imported when used."""
