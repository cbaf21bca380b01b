port = serial_port("/dev/gauge0", baud=9600, echo=False)
port.reset()
