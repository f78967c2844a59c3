#include "ui/widgets/wheel_guard.h"

#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QEvent>

namespace stillroom::ui {

namespace {

class WheelGuard : public QObject {
  public:
    using QObject::QObject;

    bool eventFilter(QObject* object, QEvent* event) override {
        const bool wheel = event->type() == QEvent::Wheel;
        if (!wheel && event->type() != QEvent::Polish) return false;
        if (qobject_cast<QComboBox*>(object) == nullptr && qobject_cast<QAbstractSpinBox*>(object) == nullptr)
            return false;
        if (wheel) {
            event->ignore(); // for the page it stands in
            return true;
        }
        auto* box = static_cast<QWidget*>(object);
        if (box->focusPolicy() == Qt::WheelFocus) box->setFocusPolicy(Qt::StrongFocus);
        return false;
    }
};

} // namespace

void guardWheel() {
    static const QString kName = QStringLiteral("wheel guard");
    if (qApp->findChild<QObject*>(kName, Qt::FindDirectChildrenOnly) != nullptr) return;
    auto* guard = new WheelGuard(qApp);
    guard->setObjectName(kName);
    qApp->installEventFilter(guard);
}

} // namespace stillroom::ui
