#include "engine/ui/window.h"

#include "engine/gl/load.h"
#include "engine/ui/autosave.h"
#include "engine/ui/desk.h"
#include "engine/ui/frame_log.h"
#include "engine/ui/input_queue.h"
#include "engine/ui/measured_wishes.h"
#include "engine/ui/recovery.h"
#include "engine/ui/screenshot.h"

#include <glad/gl.h>

#include <algorithm>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <cstdio>
#include <GLFW/glfw3.h>
#include <imgui.h>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

namespace {

using namespace ui;

constexpr double drag_budget_s = 0.012, idle_budget_s = 0.030;

struct Screen {
    GLFWwindow* window = nullptr;
    bool dirty = true; ///< what is on the glass is not ours any more
    PointerQueue pointer;
    bool held[ImGuiMouseButton_COUNT] = {}; ///< buttons, by what `pointer` has handed on
    KeyQueue keys;
    InputOrder inputs = 0;            ///< how many came so far
    double last_input_s = 0.0;        ///< when a person last did something
    float x = 0.0F, y = 0.0F;         ///< where the pointer was when the last event told
    std::vector<std::string> dropped; ///< files let go over the window, not looked at yet
};

Screen& screen_of(GLFWwindow* window) {
    return *static_cast<Screen*>(glfwGetWindowUserPointer(window));
}

float content_scale(GLFWwindow* window, double asked) {
    if (asked > 0.0) return static_cast<float>(std::clamp(asked, 0.5, 4.0));
    float x = 1.0F, y = 1.0F;
    glfwGetWindowContentScale(window, &x, &y);
    return std::clamp(std::max(x, y), 1.0F, 4.0F);
}

/// Everything is laid out in framebuffer pixels: the backend's window units are converted. One
/// press or release of the pointer is handed on, at the place where it happened.
void use_framebuffer_pixels(Screen& screen) {
    ImGuiIO& io = ImGui::GetIO();
    int width = 0, height = 0, window_width = 1, window_height = 1;
    glfwGetFramebufferSize(screen.window, &width, &height);
    glfwGetWindowSize(screen.window, &window_width, &window_height);
    io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
    io.DisplayFramebufferScale = {1, 1};
    ImVec2 at = io.MousePos;
    const bool its_turn = screen.pointer.order() < screen.keys.order();
    if (const auto event = its_turn ? screen.pointer.next(at.x, at.y) : std::nullopt)
        if (event->button >= 0 && event->button < ImGuiMouseButton_COUNT)
            screen.held[event->button] = event->down;
    // The backend asks how the buttons are by now: of a drag that began and ended during one slow
    // frame it would know nothing.
    std::copy(std::begin(screen.held), std::end(screen.held), std::begin(io.MouseDown));
    const float sx = static_cast<float>(width) / static_cast<float>(std::max(1, window_width));
    const float sy = static_cast<float>(height) / static_cast<float>(std::max(1, window_height));
    if (at.x > -1e6F) io.MousePos = {at.x * sx, at.y * sy};
}

/// Keys and what was written, as far as the pointer has come.
void hand_keys_on(Screen& screen) {
    for (const KeyEvent& e : screen.keys.next(screen.pointer.order())) {
        if (e.character != 0)
            ImGui_ImplGlfw_CharCallback(screen.window, e.character);
        else
            ImGui_ImplGlfw_KeyCallback(screen.window, e.key, e.scancode, e.action, e.mods);
    }
}

void draw(Screen& screen, FrameLog& log) {
    int width = 0, height = 0;
    glfwGetFramebufferSize(screen.window, &width, &height);
    glViewport(0, 0, width, height);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    log.done(FrameLog::Part::draw);
    glfwSwapBuffers(screen.window);
    log.done(FrameLog::Part::swap);
}

/// Pictures wait while the pointer or a key is busy with something else than a drag.
bool may_refine(const Screen& screen, const Desk& desk) {
    if (!screen.pointer.empty()) return false;
    return desk.app.dragging() || desk.app.orbit.turning ||
           glfwGetTime() - screen.last_input_s > 0.12;
}

double wait_for(const Screen& screen, const Desk& desk, int more_frames) {
    if (more_frames > 0 || !screen.pointer.empty() || !screen.keys.empty()) return 0.0;
    // The picture's own thread wakes the loop.
    if (desk.pictures->busy()) return 0.05;
    if (desk.pictures->refining() || desk.pictures->behind(desk.app))
        return may_refine(screen, desk) ? 0.0005 : 0.05;
    return desk.app.rows.editing != 0 || desk.app.files.open ? 0.5 : 30.0;
}

/// Asked to close: unsaved changes are asked about first.
void heed_close(Screen& screen, App& app) {
    if (!glfwWindowShouldClose(screen.window) || app.quit) return;
    if (!app.history.dirty()) {
        app.quit = true;
        return;
    }
    glfwSetWindowShouldClose(screen.window, GLFW_FALSE);
    app.asked = Wish{Act::quit, {}};
}

/// A set is opened, a measured distribution goes to the picked light, anything else is read as a
/// mesh; one at a time.
void heed_drop(Screen& screen, App& app) {
    if (screen.dropped.empty()) return;
    const std::string file = screen.dropped.front();
    const std::size_t count = screen.dropped.size();
    screen.dropped.clear();
    Outbox out;
    out.wish(ends_like(file, {".json"}) ? Act::open_file
             : is_measured_file(file)   ? Act::read_measured
                                        : Act::read_mesh,
             file);
    carry_out(app, out);
    if (count > 1) app.notice = "one file at a time: the first of those was taken";
}

void loop(Screen& screen, Desk& desk, double asked_scale, FrameLog& log) {
    std::uint64_t last = 0;
    int more_frames = 3;
    std::string title;
    Autosave autosave(unsaved_folder());
    while (!desk.app.quit) {
        const double wait = wait_for(screen, desk, more_frames);
        const double before = glfwGetTime();
        if (wait > 0.0)
            glfwWaitEventsTimeout(wait);
        else
            glfwPollEvents();
        // An event, not the end of the wait: focus and hover settle two frames later.
        if (wait > 0.001 && glfwGetTime() - before < wait) more_frames = 3;
        constexpr double asleep_s = 0.001;
        log.begin(wait > asleep_s && glfwGetTime() - before > asleep_s);
        heed_close(screen, desk.app);
        heed_drop(screen, desk.app);
        if (take_results(desk.app)) more_frames = std::max(more_frames, 2);
        refresh_theme(desk, content_scale(screen.window, asked_scale));
        if (desk.atlas_is_new) {
            ImGui_ImplOpenGL3_DestroyFontsTexture();
            ImGui_ImplOpenGL3_CreateFontsTexture();
            desk.atlas_is_new = false;
        }
        log.done(FrameLog::Part::results);
        if (may_refine(screen, desk) &&
            desk.pictures->work(desk.app, desk.app.dragging() ? drag_budget_s : idle_budget_s))
            log.pictured(desk.pictures->shown_revision());
        log.done(FrameLog::Part::picture);
        write_seen_picture(desk.app, *desk.pictures);
        ImGui_ImplOpenGL3_NewFrame();
        hand_keys_on(screen);
        ImGui_ImplGlfw_NewFrame();
        use_framebuffer_pixels(screen);
        ImGui::NewFrame();
        const std::uint64_t revision = desk.app.revision();
        build_frame(desk.app, desk.theme, desk.pictures->shown());
        ImGui::Render();
        if (desk.app.revision() != revision) log.changed(desk.app.revision());
        autosave.keep(desk.app);
        more_frames = std::max(0, more_frames - 1);
        const std::uint64_t hash = hash_of(*ImGui::GetDrawData(), desk.pictures->counter());
        log.done(FrameLog::Part::build);
        if (hash != last || screen.dirty) draw(screen, log);
        log.end(desk.app.dragging());
        last = hash;
        screen.dirty = false;
        const std::string wanted = desk.app.history.set().name + " – Keystead";
        if (wanted != title) glfwSetWindowTitle(screen.window, wanted.c_str());
        title = wanted;
    }
    autosave.finish();
}

void touched(GLFWwindow* window) {
    screen_of(window).last_input_s = glfwGetTime();
}

void queue_button(GLFWwindow* window, int button, int action, int) {
    // Not glfwGetCursorPos: that asks where the pointer is by now.
    Screen& screen = screen_of(window);
    screen.pointer.add({button, action == GLFW_PRESS, screen.x, screen.y, screen.inputs++});
    touched(window);
}

void moved(GLFWwindow* window, double x, double y) {
    screen_of(window).x = static_cast<float>(x);
    screen_of(window).y = static_cast<float>(y);
    touched(window);
}

/// Our own callbacks; the backend's are called from them, except that buttons and keys wait their
/// turn.
void listen(Screen& screen) {
    GLFWwindow* window = screen.window;
    glfwSetWindowUserPointer(window, &screen);
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { screen_of(w).dirty = true; });
    glfwSetFramebufferSizeCallback(window,
                                   [](GLFWwindow* w, int, int) { screen_of(w).dirty = true; });
    glfwSetMouseButtonCallback(window, queue_button);
    glfwSetCursorPosCallback(window, moved);
    glfwSetWindowFocusCallback(window, ImGui_ImplGlfw_WindowFocusCallback);
    glfwSetCursorEnterCallback(window, ImGui_ImplGlfw_CursorEnterCallback);
    glfwSetCharCallback(window, [](GLFWwindow* w, unsigned character) {
        screen_of(w).keys.add({0, 0, 0, 0, character, screen_of(w).inputs++});
        touched(w);
    });
    glfwSetScrollCallback(window, [](GLFWwindow* w, double x, double y) {
        ImGui_ImplGlfw_ScrollCallback(w, x, y);
        touched(w);
    });
    glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** files) {
        screen_of(w).dropped.assign(files, files + count);
        touched(w);
    });
    glfwSetKeyCallback(window, [](GLFWwindow* w, int key, int scancode, int action, int mods) {
        screen_of(w).keys.add({key, scancode, action, mods, 0, screen_of(w).inputs++});
        touched(w);
    });
}

GLFWwindow* open_window(const WindowOptions& options) {
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 4);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 1);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
    glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
    GLFWwindow* window =
        glfwCreateWindow(options.width_px, options.height_px, "Keystead", nullptr, nullptr);
    if (window != nullptr)
        glfwSetWindowSizeLimits(window, 800, 500, GLFW_DONT_CARE, GLFW_DONT_CARE);
    return window;
}

int run_on_screen(Screen& screen, const WindowOptions& options) {
    FrameLog log(options.frame_log);
    if (log.wanted() && !log.writes()) {
        std::fprintf(stderr, "keystead: %s: cannot be written\n", options.frame_log.c_str());
        return 2;
    }
    glfwMakeContextCurrent(screen.window);
    glfwSwapInterval(1);
    if (const Outcome problem = load_gl(glfwGetProcAddress)) {
        std::fprintf(stderr, "keystead: %s\n", problem->message().c_str());
        return 3;
    }
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().LogFilename = nullptr;
    int code = 2;
    {
        Desk desk;
        if (open_desk(desk, options, content_scale(screen.window, options.scale),
                      [] { glfwPostEmptyEvent(); })) {
            mention_left_behind(desk.app, unsaved_folder());
            listen(screen);
            ImGui_ImplGlfw_InitForOpenGL(screen.window, false);
            ImGui_ImplOpenGL3_Init("#version 410 core");
            desk.pictures = std::make_unique<PictureMaker>(options.filler);
            loop(screen, desk, options.scale, log);
            save_settings(desk.app.settings, desk.app.settings_path);
            desk.pictures.reset();
            ImGui_ImplOpenGL3_Shutdown();
            ImGui_ImplGlfw_Shutdown();
            code = 0;
        }
    }
    ImGui::DestroyContext();
    return code;
}

} // namespace

int run_window(const WindowOptions& options) {
    if (!options.screenshot.empty()) return take_screenshot(options);
    if (glfwInit() == GLFW_FALSE) {
        std::fprintf(stderr, "keystead: no screen to open a window on (is DISPLAY set?)\n");
        return 3;
    }
    Screen screen;
    screen.window = open_window(options);
    int code = 3;
    if (screen.window == nullptr) {
        std::fprintf(stderr, "keystead: the screen offers no OpenGL 4.1\n");
    } else {
        code = run_on_screen(screen, options);
        glfwDestroyWindow(screen.window);
    }
    glfwTerminate();
    return code;
}

} // namespace keystead
