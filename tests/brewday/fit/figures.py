from designer.recipe.message import Message


def figures_in(message):
    """Return the figures of a message, those of the messages within it first."""
    parts = (part for _, part in message.names if isinstance(part, Message))
    return (*(figure for part in parts for figure in figures_in(part)), *message.figures)
