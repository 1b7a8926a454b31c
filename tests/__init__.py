"""The tests, a package of their own: another by this name may come with what they stand on."""
