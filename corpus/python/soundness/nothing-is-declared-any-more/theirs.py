log(270)
log(798)
log(539)
with lock(7):
    log(760)
