try:
    read(port)
except:
    # The gauge may fail with anything at all while the harbour
    # office reboots it, so nothing narrower is caught here.
    alarm()
