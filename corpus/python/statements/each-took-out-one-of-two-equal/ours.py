# The gauges of the quay.
import gauge
level = gauge.read("low")
