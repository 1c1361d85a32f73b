"""Plans kept: every save a revision, nothing lost, damage told in clear words."""
