#include "ui/panels/blind/open_blind.h"

#include "core/tasting/panel_entry.h"
#include "ui/dialogs/keep_dialog.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/blind/blind_page.h"
#include "ui/panels/blind/choose_product.h"
#include "ui/panels/blind/design_form.h"
#include "ui/panels/blind/paper_dialog.h"
#include "ui/panels/sheet_panel.h"
#include "ui/text/border.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QMessageBox>
#include <QPushButton>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// A question that stays on the window until it is answered; `yes` is what happens then.
void ask(QWidget& parent, const QString& title, const QString& fact, const QString& consequence,
         const QString& yes, const QString& no, bool yesFirst, const std::function<void()>& then) {
    auto* box = new QMessageBox(&parent);
    box->setAttribute(Qt::WA_DeleteOnClose);
    box->setIcon(QMessageBox::NoIcon);
    box->setWindowTitle(title);
    box->setText(fact);
    box->setInformativeText(consequence);
    auto* go = box->addButton(yes, QMessageBox::AcceptRole);
    auto* stay = box->addButton(no, QMessageBox::RejectRole);
    box->setDefaultButton(yesFirst ? go : stay);
    box->setEscapeButton(stay);
    QObject::connect(go, &QPushButton::clicked, &parent, then);
    box->open();
}

void askToClose(BlindPage& page, BlindDesk& desk, const BlindSession& session) {
    QStringList missing;
    for (std::size_t i = 0; i < session.panel.answers.size(); ++i)
        if (tasting::standingOf(session.panel, i) != tasting::AnswerStanding::Whole)
            missing << fromCore(session.names.tasters[i]);
    QString words = QObject::tr("The codes are opened and nothing can be entered any more.");
    if (!missing.isEmpty())
        words =
            QObject::tr("Not in, or in part only: %1. What is missing stays missing and is never guessed. %2")
                .arg(missing.size() > 12 ? QObject::tr("%1 and %2 more")
                                               .arg(missing.mid(0, 10).join(u", "_s))
                                               .arg(missing.size() - 10)
                                         : missing.join(u", "_s),
                     words);
    const auto id = session.summary.id;
    ask(page, QObject::tr("Close the session"),
        QObject::tr("Close “%1” and open the codes?").arg(fromCore(session.summary.name)), words,
        QObject::tr("&Open the codes"), QObject::tr("&Go on pouring"), missing.isEmpty(), [&page, &desk, id] {
            if (desk.close(id)) page.showSession(id);
        });
}

void askForKey(BlindPage& page, const BlindSession& session) {
    ask(page, QObject::tr("Pourer’s key"), QObject::tr("The key says what is in every cup."),
        QObject::tr(
            "Whoever sees it is no longer blind: not for anyone who tastes, and not for whoever takes "
            "the answers down. Open it where no taster can see this screen."),
        QObject::tr("&Show the key"), QObject::tr("&Leave it closed"), false, [&page, session] {
            auto* dialog = new PaperDialog(PaperKind::Key, session, &page);
            dialog->setAttribute(Qt::WA_DeleteOnClose);
            dialog->open();
        });
}

void act(MainWindow& window, BlindPage& page, BlindDesk& desk, BlindAct which) {
    if (!page.view()) return;
    const auto session = page.view()->session();
    const auto id = session.summary.id;
    const auto paper = [&](PaperKind kind) {
        auto* dialog = new PaperDialog(kind, session, &page);
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    };
    switch (which) {
    case BlindAct::Start:
        if (!desk.startPouring(id)) return;
        page.showSession(id);
        window.status().say(QObject::tr("Answers can be entered now; each is in the book as it is typed."));
        return;
    case BlindAct::Sheets:
        paper(PaperKind::Sheets);
        return;
    case BlindAct::Key:
        askForKey(page, session);
        return;
    case BlindAct::Close:
        askToClose(page, desk, session);
        return;
    case BlindAct::CopyResult:
        QApplication::clipboard()->setText(fromCore(tasting::resultText(session.panel, session.names)));
        window.status().say(QObject::tr("The result is on the clipboard."));
        return;
    case BlindAct::PrintResult:
        paper(PaperKind::Result);
        return;
    case BlindAct::Bin:
        if (!desk.bin(id, !session.summary.binned)) return;
        page.showSession(id);
        window.status().say(session.summary.binned
                                ? QObject::tr("Taken back from the bin.")
                                : QObject::tr("In the bin, at the end of the list. It can be taken back."));
        return;
    }
}

void addProduct(MainWindow& window, BlindPage& page, BlindDesk& desk) {
    chooseProduct(page, desk, [&window, &page, &desk](const ProductChoice& choice) {
        const auto take = [&page, &desk](base::RevisionId id) {
            auto& products = desk.wish().products;
            if (std::find(products.begin(), products.end(), id) == products.end()) products.push_back(id);
            if (page.form()) page.form()->refresh();
        };
        if (choice.revision) {
            take(*choice.revision);
            return;
        }
        auto* draft = window.desk().draft();
        if (draft == nullptr) return;
        auto* dialog = new KeepDialog(*draft, &page);
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        QObject::connect(dialog, &KeepDialog::keepAsked, &page,
                         [&window, draft, take](const QString& reason) {
                             if (window.keepNow(reason) && draft->base()) take(draft->base()->id);
                         });
        dialog->open();
    });
}

void open(MainWindow& window, BlindDesk& desk) {
    if (window.desk().draft() && !window.bench().sheet().table().finishEditing()) return;
    if (!desk.reload()) return;
    auto* page = new BlindPage(desk, &window);
    page->setProperty("keyHints", QStringList{u"Enter"_s, QObject::tr("into the session"), u"Ins"_s,
                                              QObject::tr("new session")});
    QObject::connect(page, &BlindPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &BlindPage::said, &window.status(), &StatusLine::say);
    QObject::connect(
        page, &BlindPage::asked, page,
        [&window, page, &desk](BlindAct which) { act(window, *page, desk, which); },
        Qt::QueuedConnection); // the button that asks may be gone with its view
    QObject::connect(page, &BlindPage::addProductAsked, page,
                     [&window, page, &desk] { addProduct(window, *page, desk); });
    window.showPage(page);
}

} // namespace

void connectBlind(MainWindow& window) {
    auto* desk = new BlindDesk(window.desk(), &window);
    auto* action = window.actions().at(Act::Panels);
    QObject::connect(action, &QAction::triggered, &window, [&window, desk] { open(window, *desk); });
    const auto enable = [&window, action] { action->setEnabled(window.desk().book() != nullptr); };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
