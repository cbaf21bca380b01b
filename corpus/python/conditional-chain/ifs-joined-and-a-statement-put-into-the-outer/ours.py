def a():
    if level > 3 and warn:
        publish_warning(level)
