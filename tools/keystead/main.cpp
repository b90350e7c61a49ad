#include <cstdio>

int main() {
    std::puts(KEYSTEAD_VERSION);
    return 0;
}
