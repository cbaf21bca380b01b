def close(server):
    if server.feed is not None:
        # Put off the end of the feed by one round:
        # gauges that report late would find it closed.

        server.feed.add_callback(server.feed.stop)
        server.join()
