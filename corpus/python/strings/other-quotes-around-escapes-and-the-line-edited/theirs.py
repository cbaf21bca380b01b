def show(level):
    print('low\t' + level.text + '\r\n')
    print('the "low" of the tide', level)
    return level.replace('\\', '//')
