def stamp(match, form):
    when = None
    if match:
        when = time.mktime(time.strptime(match.group("when"), form))
    return when
