"""SVG to PNG, with the shipped font and nothing of the machine's own."""

from firstfix.documents.drawing.kit import font

LARGEST_SCALE = 10.0
_DOTS_PER_INCH = 72.0


def png(svg: str, scale: float = 2.0) -> bytes:
    """The PNG of one of our drawings, `scale` pixels to a point: 2 is 144 dots per inch. The same bytes for the same SVG.

    Raises ValueError for a scale that is not above 0 and at most 10, and for what is no SVG.
    """
    if not 0 < scale <= LARGEST_SCALE:
        raise ValueError(f"a scale is above 0 and at most {LARGEST_SCALE:g}, not {scale:g}")
    import resvg_py

    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg,
            zoom=scale,
            dpi=_DOTS_PER_INCH,
            skip_system_fonts=True,
            font_files=[str(font.REGULAR), str(font.BOLD)],
            font_family=font.FAMILY,
            sans_serif_family=font.FAMILY,
            background="#ffffff",
        )
    )
