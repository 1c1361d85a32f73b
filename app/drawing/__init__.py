"""SVG of a plan: overlays, symbols and sheets, written with svgwrite."""
