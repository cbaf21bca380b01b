def a():
    if level > 3:
        record_level(level)
        if warn:
            publish_warning(level)
