#include "tests/window/drop.h"

#include "tests/window/wait.h"

#include <initializer_list>

// Last: its macros would change other headers.
#include <X11/Xatom.h>
#include <X11/Xlib.h>

namespace keystead::journeys {

namespace {

struct Source {
    ::Display* display;
    Window own, target;

    Atom atom(const char* name) const { return XInternAtom(display, name, False); }

    void tell(const char* message, std::initializer_list<long> words) const {
        XEvent event{};
        event.xclient.type = ClientMessage;
        event.xclient.window = target;
        event.xclient.message_type = atom(message);
        event.xclient.format = 32;
        int i = 0;
        for (const long word : words) event.xclient.data.l[i++] = word;
        XSendEvent(display, target, False, NoEventMask, &event);
        XFlush(display);
    }

    /// The next event that belongs to us, if there is one.
    bool next(XEvent& event) const {
        while (XPending(display) > 0) {
            XNextEvent(display, &event);
            if (event.xany.window == own) return true;
        }
        return false;
    }

    /// Waits for the target's message. Its second word is its yes: bit 0 by the protocol; GLFW
    /// puts the length of what it took there in the end.
    bool agreed(const char* message, const std::string& address) const {
        const Atom wanted = atom(message);
        bool yes = false;
        const bool came = within(patience_s, [&] {
            XEvent event;
            while (next(event)) {
                if (event.type == SelectionRequest) hand_over(event.xselectionrequest, address);
                if (event.type != ClientMessage || event.xclient.message_type != wanted) continue;
                yes = event.xclient.data.l[1] != 0;
                return true;
            }
            return false;
        });
        return came && yes;
    }

    void hand_over(const XSelectionRequestEvent& asked, const std::string& address) const {
        XChangeProperty(display, asked.requestor, asked.property, asked.target, 8, PropModeReplace,
                        reinterpret_cast<const unsigned char*>(address.data()),
                        static_cast<int>(address.size()));
        XEvent answer{};
        answer.xselection.type = SelectionNotify;
        answer.xselection.requestor = asked.requestor;
        answer.xselection.selection = asked.selection;
        answer.xselection.target = asked.target;
        answer.xselection.property = asked.property;
        answer.xselection.time = asked.time;
        XSendEvent(display, asked.requestor, False, NoEventMask, &answer);
        XFlush(display);
    }
};

} // namespace

bool drop_file(::Display* display, Window target, const std::filesystem::path& file, int x, int y) {
    const Window own =
        XCreateSimpleWindow(display, DefaultRootWindow(display), -10, -10, 1, 1, 0, 0, 0);
    const Source source{display, own, target};
    const std::string address = "file://" + file.string() + "\r\n";
    XSetSelectionOwner(display, source.atom("XdndSelection"), own, CurrentTime);
    constexpr long version = 5;
    const long self = static_cast<long>(own);
    source.tell("XdndEnter",
                {self, version << 24, static_cast<long>(source.atom("text/uri-list"))});
    source.tell("XdndPosition", {self, 0, (static_cast<long>(x) << 16) | y, CurrentTime,
                                 static_cast<long>(source.atom("XdndActionCopy"))});
    bool taken = source.agreed("XdndStatus", address);
    if (taken) {
        source.tell("XdndDrop", {self, 0, CurrentTime});
        taken = source.agreed("XdndFinished", address);
    }
    XDestroyWindow(display, own);
    XFlush(display);
    return taken;
}

} // namespace keystead::journeys
