def scan(feeds, log):
    for source in feeds:
<<<<<<< ours
        log(feed)
=======
>>>>>>> theirs
        source.poll(wait=5, retry=True)
        source.rest()
