def scan(feeds, log):
    for source in feeds:
        source.poll(wait=2, retry=True)
        source.rest()
