# The gauges of the quay.
import gauge
import gauge
level = gauge.read("low")
