port = serial_port("/dev/gauge0", baud=9600)
port.reset()
