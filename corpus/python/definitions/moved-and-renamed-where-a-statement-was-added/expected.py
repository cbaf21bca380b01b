def active_gauges():
    '''
    Return the gauges that answered within the last minute
    '''
    _cleanup()
    return list(_gauges)

depth = compute(58)

def level_now(port='harbour'):
    '''
    Return the level that the gauge in the harbour shows now
    '''
    return _current_level

def parent_board():
    '''
    Return the board that this one belongs to
    '''
    return _parent_board
