"""When it will be finished: the whole remaining job played through many times."""
