def stamp(match, form):
    when = None
    if match:
        when = int(time.mktime(time.strptime(match.group("when"),
                                             form)))
    return when
