#include "tests/window/child.h"

#include "tests/window/wait.h"

#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utility>

namespace keystead::journeys {

namespace {

[[noreturn]] void become(const std::vector<std::string>& words, const ChildOptions& options) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    for (const auto& [name, value] : options.environment) {
        if (value.empty())
            unsetenv(name.c_str());
        else
            setenv(name.c_str(), value.c_str(), 1);
    }
    if (!options.folder.empty() && chdir(options.folder.c_str()) != 0) _exit(127);
    const char* log = options.log.empty() ? "/dev/null" : options.log.c_str();
    const int out = open(log, O_WRONLY | O_CREAT | O_APPEND, 0644),
              in = open("/dev/null", O_RDONLY);
    dup2(in, 0), dup2(out, 1), dup2(out, 2);
    if (options.kept_descriptor > 2) fcntl(options.kept_descriptor, F_SETFD, 0);
    std::vector<char*> arguments;
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    execvp(arguments[0], arguments.data());
    _exit(127);
}

} // namespace

Child::Child(const std::vector<std::string>& words, const ChildOptions& options) {
    pid_ = fork();
    if (pid_ == 0) become(words, options);
}

Child::Child(Child&& other) noexcept
    : pid_(std::exchange(other.pid_, -1))
    , status_(other.status_) {}

Child& Child::operator=(Child&& other) noexcept {
    if (this == &other) return *this;
    kill_now();
    pid_ = std::exchange(other.pid_, -1);
    status_ = other.status_;
    return *this;
}

bool Child::reap(int flags) {
    if (pid_ <= 0) return true;
    int status = 0;
    if (waitpid(pid_, &status, flags) != pid_) return false;
    status_ = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    pid_ = -1;
    return true;
}

bool Child::running() {
    return !reap(WNOHANG);
}

int Child::status_within(double limit_s) {
    return within(limit_s, [&] { return !running(); }) ? status_ : -1;
}

void Child::kill_now() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    reap(0);
}

} // namespace keystead::journeys
