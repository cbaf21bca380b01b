log(270)
log(798)
log(760)
level = 732
