#include "ui/session/impact_reading.h"

#include "core/store/where_used.h"
#include "ui/session/workbook_session.h"

#include <QMetaObject>

#include <algorithm>
#include <chrono>
#include <set>

namespace stillroom::ui {

using base::IngredientId;
using Time = std::chrono::steady_clock;

struct ImpactReading::Question {
    int number = 0;
    bool fresh = false; // drafts are read anew
    IngredientId ingredient;
    preparation::LarderEdit edit;  // empty: only where it is used
    std::vector<larder::Lot> lots; // that go with it
    preparation::Side now;
    Time::time_point asked;
};

// What was read of the book. Only the worker touches it.
struct ImpactReading::Kept {
    std::unordered_map<base::RevisionId, std::shared_ptr<const UsedSpec>> revisions;
    std::unordered_map<base::DraftId, std::shared_ptr<const UsedSpec>> drafts;

    std::shared_ptr<const UsedSpec> read(const store::Workbook& book, const store::IngredientUse& use) {
        if (use.revision) {
            auto& known = revisions[*use.revision];
            if (!known)
                if (auto revision = book.revision(*use.revision))
                    known = std::make_shared<const UsedSpec>(
                        UsedSpec{use.drink, false, revision->number, std::move(revision->spec)});
            return known;
        }
        if (!use.draft) return nullptr;
        auto& known = drafts[*use.draft];
        if (!known)
            if (auto draft = book.draft(*use.draft))
                known =
                    std::make_shared<const UsedSpec>(UsedSpec{use.drink, true, 0, std::move(draft->spec)});
        return known;
    }
};

ImpactReading::ImpactReading(WorkbookSession& book)
    : m_book(book),
      m_kept(std::make_unique<Kept>()),
      m_worker([this] { work(); }) {}

ImpactReading::~ImpactReading() {
    {
        const std::lock_guard lock(m_mutex);
        m_stop = true;
        m_cancel = true;
        m_next.reset();
    }
    m_wake.notify_one();
    m_worker.join();
}

void ImpactReading::refresh() {
    const std::lock_guard lock(m_mutex);
    m_fresh = true; // told with the next question: what the worker keeps is its own
}

void ImpactReading::askUses(IngredientId ingredient) {
    Question question;
    question.ingredient = ingredient;
    put(std::move(question));
}

void ImpactReading::ask(const preparation::LarderEdit& edit, const std::vector<larder::Lot>& lots) {
    if (edit.empty()) return;
    Question question;
    question.ingredient = edit.front().id;
    question.edit = edit;
    question.lots = lots;
    put(std::move(question));
}

void ImpactReading::put(Question question) {
    question.now = {m_book.larder(), m_book.houseRules()};
    question.asked = Time::now();
    question.number = ++m_last;
    ++m_open;
    const std::lock_guard lock(m_mutex);
    question.fresh = std::exchange(m_fresh, false);
    if (m_next) {
        question.fresh |= m_next->fresh;
        --m_open; // it is never answered
    }
    m_cancel = true;
    m_next = std::make_unique<Question>(std::move(question));
    m_wake.notify_one();
}

void ImpactReading::cancel() {
    ++m_last; // whatever is under way is not told
    m_cancel = true;
}

void ImpactReading::work() {
    while (true) {
        std::unique_ptr<Question> question;
        {
            std::unique_lock lock(m_mutex);
            m_wake.wait(lock, [this] { return m_stop || m_next; });
            if (m_stop) return;
            question = std::move(m_next);
            m_cancel = false;
        }
        try {
            answer(*question);
        } catch (const store::StoreError&) {
            QMetaObject::invokeMethod(
                this, [this] { Q_EMIT failed(); }, Qt::QueuedConnection);
        }
        QMetaObject::invokeMethod(
            this, [this] { --m_open; }, Qt::QueuedConnection);
    }
}

void ImpactReading::answer(const Question& question) {
    const store::Workbook& book = m_book.book();
    if (question.fresh) m_kept->drafts.clear();
    const preparation::Specs preparations = book.preparations();
    std::set<base::DrinkId> preparationDrinks;
    for (const auto& [id, spec] : preparations)
        if (const auto* made = question.now.larder.find(id); made != nullptr && made->madeBy)
            preparationDrinks.insert(*made->madeBy);
    const auto tell = [this, number = question.number](auto call) {
        QMetaObject::invokeMethod(
            this,
            [this, number, call] {
                if (number == m_last) call();
            },
            Qt::QueuedConnection);
    };

    auto uses = std::make_shared<UsesFound>();
    uses->ingredient = question.ingredient;
    const preparation::Followers followers(question.now.larder, preparations);
    const auto touched = question.edit.empty() ? followers.of({question.ingredient})
                                               : preparation::touchedBy(question.now.larder, question.edit,
                                                                        preparations, question.lots);
    auto where = store::whereUsed(book, question.ingredient, touched, followers);
    const auto found = std::move(where.places);
    for (const store::IngredientUse& use : found) {
        ++(use.draft ? uses->drafts : uses->revisions);
        if (use.draft &&
            std::find(uses->inDrafts.begin(), uses->inDrafts.end(), use.drink) == uses->inDrafts.end())
            uses->inDrafts.push_back(use.drink);
    }
    uses->by = std::move(where.by);
    for (const preparation::Use& use : uses->by)
        uses->preparations += preparationDrinks.count(use.by) > 0 ? 1 : 0;
    tell([this, preparations, counts = std::make_shared<const UsesFound>(*uses)] {
        m_preparations = preparations;
        Q_EMIT usesFound(counts);
    });

    std::vector<std::shared_ptr<const UsedSpec>> specs;
    specs.reserve(found.size());
    for (const store::IngredientUse& use : found) {
        if (m_cancel) return;
        if (auto spec = m_kept->read(book, use)) specs.push_back(std::move(spec));
    }
    if (question.edit.empty()) {
        uses->specs = std::move(specs);
        tell([this, uses] { Q_EMIT usesFound(uses); });
        return;
    }
    auto answer = std::make_shared<ImpactFound>();
    answer->subjects = std::move(specs);
    answer->edit = question.edit;
    std::vector<preparation::ImpactSubject> subjects;
    subjects.reserve(answer->subjects.size());
    for (const auto& used : answer->subjects)
        subjects.push_back({&used->spec, nullptr});
    answer->impact = preparation::editImpact(question.now, question.edit, preparations, subjects, &m_cancel,
                                             question.lots);
    if (!answer->impact.drinks.complete) return;
    answer->milliseconds = std::chrono::duration<double, std::milli>(Time::now() - question.asked).count();
    tell([this, answer] { Q_EMIT impactFound(answer); });
}

} // namespace stillroom::ui
