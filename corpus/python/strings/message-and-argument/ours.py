log.warning("no data from feed %s", feed.name)
feed.restart()
