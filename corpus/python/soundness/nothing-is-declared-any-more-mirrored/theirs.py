log(270)
level = 732
log(798)
log(539)
log(level + 46)
log(760)
