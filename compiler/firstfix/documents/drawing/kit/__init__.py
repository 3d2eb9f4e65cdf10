"""What every sheet is made of: SVG elements, the font, the palette, the page with its title and key, and PNG of it."""
