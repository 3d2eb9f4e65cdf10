"""From the network as it stands to the network as planned: steps in an order in which as little as possible goes down."""
