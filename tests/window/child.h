// A program started by a test. It never outlives the test, even if that is killed.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <sys/types.h>

namespace keystead::journeys {

struct ChildOptions {
    std::map<std::string, std::string> environment; ///< added; an empty value takes it away
    std::string folder;                             ///< to start in; empty: the test's own
    std::string log;                                ///< stdout and stderr go there; empty: nowhere
    int kept_descriptor = -1;                       ///< stays open in it
};

class Child {
public:
    Child() = default;
    /// `words[0]` is looked for on PATH. One that cannot be started ends with status 127.
    explicit Child(const std::vector<std::string>& words, const ChildOptions& options = {});
    ~Child() { kill_now(); }
    Child(Child&& other) noexcept;
    Child& operator=(Child&& other) noexcept;

    pid_t pid() const { return pid_; }
    bool running();
    /// Its exit status, 128 + the signal that ended it, or -1 after `limit_s`.
    int status_within(double limit_s);
    void kill_now(); ///< SIGKILL, and waits for its end

private:
    bool reap(int flags);
    pid_t pid_ = -1;
    int status_ = -1;
};

} // namespace keystead::journeys
