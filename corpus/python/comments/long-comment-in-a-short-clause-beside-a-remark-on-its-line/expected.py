try:
    read(port)
except:  # noqa: E722
    # The gauge may fail with anything at all while the harbour
    # office reboots it, so nothing narrower is caught here.
    alarm()
