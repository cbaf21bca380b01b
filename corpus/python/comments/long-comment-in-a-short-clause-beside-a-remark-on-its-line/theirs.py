try:
    read(port)
except:  # noqa: E722
    alarm()
