"""What every sheet is made of: SVG elements in roles, the font, the palette and its themes, the page with its title, key, references to
other sheets and foot, the signs that sheets share; and PNG and PDF of it."""
