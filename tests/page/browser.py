"""A headless Chromium, driven through its debugging pipe (Chrome DevTools Protocol): no library beyond Python's own."""
import json, os, shutil, subprocess, tempfile, time

KEYS = {"Tab": 9, "Enter": 13, " ": 32, "End": 35, "Home": 36, "ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40}


class Browser:
    def __init__(self):
        self.profile = tempfile.mkdtemp(prefix="page_check_")
        to_read, self.write = os.pipe()
        self.read, to_write = os.pipe()
        # The pipe is at descriptors 3 and 4 of the browser.
        command = ("exec chromium --headless=new --no-sandbox --disable-gpu --hide-scrollbars --no-first-run --disable-extensions "
                   "--remote-debugging-pipe --user-data-dir=%s about:blank 3<&%d 4>&%d" % (self.profile, to_read, to_write))
        # Its own log is of no interest, and a shell may not name descriptors above 9 directly.
        self.process = subprocess.Popen(["bash", "-c", command], pass_fds=(to_read, to_write), stdin=subprocess.DEVNULL,
                                        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_read)
        os.close(to_write)
        self.rest, self.last, self.events = b"", 0, []

    def message(self):
        while b"\0" not in self.rest:
            more = os.read(self.read, 1 << 20)
            if not more:
                raise SystemExit("the browser has ended")
            self.rest += more
        one, self.rest = self.rest.split(b"\0", 1)
        return json.loads(one)

    def call(self, method, session=None, **given):
        self.last += 1
        asked = {"id": self.last, "method": method, "params": given}
        if session:
            asked["sessionId"] = session
        text = json.dumps(asked).encode() + b"\0"
        while text:
            text = text[os.write(self.write, text):]
        while True:
            told = self.message()
            if told.get("id") == self.last:
                if "error" in told:
                    raise RuntimeError("%s: %s" % (method, told["error"]["message"]))
                return told["result"]
            self.events.append(told)

    def close(self):
        try:
            self.call("Browser.close")
        except (SystemExit, OSError):
            pass
        self.process.wait(timeout=20)
        shutil.rmtree(self.profile, ignore_errors=True)


class Tab:
    """A page that is open."""

    def __init__(self, browser, url, width=1280, height=900, dark=False, ready="document.documentElement.dataset.ready === 'yes'"):
        self.browser = browser
        target = browser.call("Target.createTarget", url="about:blank")["targetId"]
        self.target = target
        self.session = browser.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Accessibility"):
            self.call(domain + ".enable")
        self.look(width, height, dark)
        self.call("Page.navigate", url=url)
        self.wait(ready)

    def call(self, method, **given):
        return self.browser.call(method, self.session, **given)

    def look(self, width, height, dark):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)
        self.call("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])

    def run(self, program):
        """The value of an expression; a promise is waited for."""
        told = self.call("Runtime.evaluate", expression=program, awaitPromise=True, returnByValue=True, userGesture=True)
        if "exceptionDetails" in told:
            details = told["exceptionDetails"]
            raise RuntimeError(details.get("exception", {}).get("description", details["text"]) + "\nwhile it ran " + program[:300])
        return told["result"].get("value")

    def wait(self, condition, seconds=60):
        end = time.time() + seconds
        while not self.run("(() => { try { return !!(%s); } catch { return false; } })()" % condition):
            if time.time() > end:
                raise RuntimeError("waited in vain for " + condition)
            time.sleep(0.05)

    def settle(self):
        """Until what was asked for is drawn."""
        self.run("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(0))))")

    def key(self, name, shift=False):
        given = {"key": name, "code": "Space" if name == " " else name, "windowsVirtualKeyCode": KEYS[name], "modifiers": 8 if shift else 0}
        text = {"Enter": "\r", " ": " "}.get(name)
        self.call("Input.dispatchKeyEvent", type="keyDown" if text else "rawKeyDown", **given, **({"text": text} if text else {}))
        self.call("Input.dispatchKeyEvent", type="keyUp", **given)

    def type(self, text):
        self.call("Input.insertText", text=text)

    def picture(self, path, whole=True):
        import base64
        told = self.call("Page.captureScreenshot", format="png", captureBeyondViewport=whole, **({"clip": self.all()} if whole else {}))
        with open(path, "wb") as f:
            f.write(base64.b64decode(told["data"]))

    def all(self):
        size = self.call("Page.getLayoutMetrics")["cssContentSize"]
        return {"x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1}

    def close(self):
        self.browser.call("Target.closeTarget", targetId=self.target)
