"""The only door for the command line and the page: one module a command, nothing imported until it is called."""
