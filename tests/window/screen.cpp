#include "tests/window/screen.h"

#include "tests/window/child.h"
#include "tests/window/drop.h"
#include "tests/window/wait.h"

#include <unistd.h>

// Last: its macros would change other headers.
#include <X11/Xatom.h>
#include <X11/Xlib.h>
#include <X11/Xutil.h>

namespace keystead::journeys {

struct Screen::Data {
    Child server;
    ::Display* display = nullptr;
    std::string name;
    int width = 0, height = 0;

    /// The mapped child of the root that is on top: there is no window manager between.
    Window top() const {
        Window root = 0, parent = 0, found = 0;
        Window* children = nullptr;
        unsigned count = 0;
        if (XQueryTree(display, DefaultRootWindow(display), &root, &parent, &children, &count) == 0)
            return 0;
        for (unsigned i = 0; i < count; ++i) {
            XWindowAttributes attributes;
            if (XGetWindowAttributes(display, children[i], &attributes) != 0 &&
                attributes.map_state == IsViewable)
                found = children[i];
        }
        if (children != nullptr) XFree(children);
        return found;
    }
};

namespace {

bool is_on_path(const char* program) {
    return Child({program, "-version"}).status_within(patience_s) != 127;
}

/// A window may be gone between two questions about it; that is no error here.
int ignore(::Display*, XErrorEvent*) {
    return 0;
}

} // namespace

Screen::Screen(int width_px, int height_px)
    : data_(std::make_unique<Data>()) {
    if (!is_on_path("xdotool")) FAIL("xdotool is missing: install the Debian package xdotool");
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    ChildOptions options;
    options.kept_descriptor = ends[1];
    const std::string size = std::to_string(width_px) + "x" + std::to_string(height_px) + "x24";
    data_->server = Child({"Xvfb", "-displayfd", std::to_string(ends[1]), "-screen", "0", size,
                           "-dpi", "96", "-nolisten", "tcp"},
                          options);
    close(ends[1]);
    char number[16] = {};
    const ssize_t got = read(ends[0], number, sizeof number - 1);
    close(ends[0]);
    if (got <= 0) FAIL("Xvfb could not be started: install the Debian package xvfb");
    data_->name = ":" + std::to_string(std::atoi(number));
    data_->width = width_px, data_->height = height_px;
    XSetErrorHandler(ignore);
    wait_for("the screen " + data_->name, [&] {
        data_->display = XOpenDisplay(data_->name.c_str());
        return data_->display != nullptr;
    });
}

Screen::~Screen() {
    if (data_->display != nullptr) XCloseDisplay(data_->display);
}

const std::string& Screen::name() const {
    return data_->name;
}
int Screen::width() const {
    return data_->width;
}
int Screen::height() const {
    return data_->height;
}

std::string Screen::title() const {
    const Window window = data_->top();
    if (window == 0) return {};
    Atom type = 0;
    int format = 0;
    unsigned long count = 0, left = 0;
    unsigned char* bytes = nullptr;
    const Atom name = XInternAtom(data_->display, "_NET_WM_NAME", False);
    if (XGetWindowProperty(data_->display, window, name, 0, 1024, False, AnyPropertyType, &type,
                           &format, &count, &left, &bytes) != Success ||
        bytes == nullptr)
        return {};
    const std::string title(reinterpret_cast<char*>(bytes), count);
    XFree(bytes);
    return title;
}

void Screen::focus() const {
    if (const Window window = data_->top(); window != 0)
        XSetInputFocus(data_->display, window, RevertToPointerRoot, CurrentTime);
    XSync(data_->display, False);
}

RgbaImage Screen::seen() const {
    return seen({0, 0, static_cast<float>(data_->width), static_cast<float>(data_->height)});
}

RgbaImage Screen::seen(const ui::Rect& part) const {
    RgbaImage image;
    image.width = static_cast<int>(part.w), image.height = static_cast<int>(part.h);
    XImage* pixels =
        XGetImage(data_->display, DefaultRootWindow(data_->display), static_cast<int>(part.x),
                  static_cast<int>(part.y), static_cast<unsigned>(image.width),
                  static_cast<unsigned>(image.height), AllPlanes, ZPixmap);
    REQUIRE(pixels != nullptr);
    image.pixels.reserve(4U * static_cast<std::size_t>(image.width) *
                         static_cast<std::size_t>(image.height));
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const unsigned long code = XGetPixel(pixels, x, y);
            for (const unsigned shift : {16U, 8U, 0U})
                image.pixels.push_back(static_cast<std::uint8_t>((code >> shift) & 0xFFU));
            image.pixels.push_back(255);
        }
    XDestroyImage(pixels);
    return image;
}

bool Screen::drop(const std::filesystem::path& file, int x, int y) const {
    return drop_file(data_->display, data_->top(), file, x, y);
}

Screen& the_screen() {
    static Screen screen(1280, 720);
    return screen;
}

} // namespace keystead::journeys
