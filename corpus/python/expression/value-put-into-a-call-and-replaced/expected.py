def stamp(match, form):
    when = None
    if match:
<<<<<<< ours
        when = int(time.mktime(time.strptime(match.group("when"),
                                             form)))
=======
        when = datetime.strptime(match.group("when"),
                                             form)
>>>>>>> theirs
        if ZONE:
            when = when.replace(tzinfo=ZONE)
    return when
