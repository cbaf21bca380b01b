log.warning("no data from feed %s", feed.title, stacklevel=2)
feed.restart()
