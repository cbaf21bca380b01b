def close(server):
    if server.feed is not None:
        # Put off the end of the feed by several rounds:
        # gauges that report late would find it closed.
        def stop_slowly():
            # One round is enough for most harbours.
            for _ in range(5):
                server.feed.wait()
            server.feed.stop()
        server.feed.add_callback(stop_slowly)
        server.join()
