log.warning("feed %s is late", feed.title, stacklevel=2)
feed.restart()
