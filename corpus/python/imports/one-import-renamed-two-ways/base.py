import tideboard.feeds
