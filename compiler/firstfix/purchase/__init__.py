"""From the build to what must be bought, in packs as sold, and what is there already."""
