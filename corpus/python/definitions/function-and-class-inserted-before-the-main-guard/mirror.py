def run(port):
    print(port)


class Ticker:
    period = 60

    def tick(self):
        self.period -= 1


def usage():
    print("tideboard PORT")


if __name__ == "__main__":
    run("dover")
