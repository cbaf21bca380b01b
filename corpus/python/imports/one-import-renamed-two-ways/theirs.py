import tideboard.sources
