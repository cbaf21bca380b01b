def show(level):
    raise TideError(u'no level of '
        u'%r today' % level)


def low(day):
    return 'low'
