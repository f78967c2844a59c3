#pragma once

namespace stillroom::app {

// True when a platform is named or a display is set. It may still not answer: see FatalExit.
bool hasDisplay();

// Qt aborts the process when it cannot reach a display. While one of these lives, it says what happened and
// leaves with kWrongUsage instead. Qt's lesser remarks about the platform are not passed on.
class FatalExit {
  public:
    FatalExit();
    ~FatalExit();
    FatalExit(const FatalExit&) = delete;
    FatalExit& operator=(const FatalExit&) = delete;
};

} // namespace stillroom::app
