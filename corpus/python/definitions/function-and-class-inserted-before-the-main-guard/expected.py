def run(port):
    print(port)


def usage():
    print("tideboard PORT")


class Ticker:
    period = 60

    def tick(self):
        self.period -= 1


if __name__ == "__main__":
    run("dover")
