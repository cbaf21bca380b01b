from tideboard import feeds

feeds.start()
