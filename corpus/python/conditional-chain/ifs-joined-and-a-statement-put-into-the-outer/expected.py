def a():
<<<<<<< ours
    if level > 3 and warn:
        publish_warning(level)
=======
    if level > 3:
        record_level(level)
        if warn:
            publish_warning(level)
>>>>>>> theirs
