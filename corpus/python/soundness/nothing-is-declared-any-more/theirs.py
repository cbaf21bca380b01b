log(270)
log(798)
with lock(7):
    log(760)
