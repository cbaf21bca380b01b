log.warning("feed %s is late", feed.name)
feed.restart()
