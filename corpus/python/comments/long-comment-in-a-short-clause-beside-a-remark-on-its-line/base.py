try:
    read(port)
except:
    alarm()
