"""Plans the material of small plywood boats."""
