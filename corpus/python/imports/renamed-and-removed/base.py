from tideboard import charts, feeds

feeds.start()
